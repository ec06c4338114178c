"""What authors are told about their entries. A rule yields findings; the page of each code stands beside its rule."""
