"""The faults there are: a file a family, each with the rows of its kinds and the places they can be at."""
