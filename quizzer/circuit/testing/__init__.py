"""What instruments read of a circuit, what results are held to, and what a reading leaves of the suspects."""
