"""What a trainee sees: one handler a file."""
