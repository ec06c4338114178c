"""What a page is made of: frozen values that say what is said and in which role, never how it looks."""
