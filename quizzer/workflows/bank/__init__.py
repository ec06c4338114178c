"""The bank as people see it: at a glance, one question, checked, searched, signed off."""
