"""The built-in dentition: crowns from parameters, set up in arches, settled into MI."""
