"""What is said, once: a value becomes a page of blocks, for terminal, paper and web alike."""
