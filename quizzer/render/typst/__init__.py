"""Tagged PDF, set with Typst: reports from blocks, and the documents of a paper."""
