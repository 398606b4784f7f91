"""A table of the forms in which designers write, with what each uses and makes, and what the checker reads of it."""
