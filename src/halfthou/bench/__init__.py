"""At the machine: the record of what was cut and read, and the next cut that follows from it."""
