"""From blocks to a medium (terminal, typst, svg, html), and what leaves for other programs (qti, csv, calendars)."""
