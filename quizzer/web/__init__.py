"""The page in a browser: routes, forms in, pages out; no rules of study, no SQL, no wording of what is told."""
