"""Forms as QTI packages for learning platforms."""
