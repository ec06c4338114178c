"""Pages as fragments of HTML: semantic, escaped, without styles or scripts."""
