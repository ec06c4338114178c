"""Study and mock-exam engine for wiring regulations. Nothing inside takes a name from here."""
