"""Work turned on the lathe: the lump, the cuts, their order, and how it is held."""
