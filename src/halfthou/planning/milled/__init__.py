"""Work cut from the solid on the mill, and what is milled on turned work."""
