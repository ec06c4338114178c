"""Understanding marks: what a paper's answers say about the people, the questions and the paper. Pure.

Marks are whole numbers of right answers; a table of marks has one row a person and one column a question, 1 for right.
Variances divide by the number of people unless it is said otherwise.
"""
