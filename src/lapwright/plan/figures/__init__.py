"""One calculation by itself, for a question asked on the roof: options as data, texts in, numbers and steps out."""
