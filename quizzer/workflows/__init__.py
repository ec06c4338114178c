"""What a person does: study, look at a question, see the bank, ask how it stands."""
