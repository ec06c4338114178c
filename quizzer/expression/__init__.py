"""A small arithmetic language for bank files, and the readers of its trees.

`reading` makes a tree from text, `evaluation` computes it, `showing` writes it for people, `mutants` bends it.
"""
