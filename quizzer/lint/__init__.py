"""What authors are told about their entries. A rule looks at an entry and yields issues; its docstring is its page."""
