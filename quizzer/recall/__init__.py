"""What is remembered: recall of topics, the mark to expect, and which entry is worth asking next. Pure."""
