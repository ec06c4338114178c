"""Mock papers: made, printed, sat, marked and reported."""
