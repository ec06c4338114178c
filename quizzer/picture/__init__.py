"""Pictures of the trade: from what a question gives to a drawing and its spoken words."""
