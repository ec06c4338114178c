"""Scans and photographs of answer sheets: from a file to what was marked in each box."""
