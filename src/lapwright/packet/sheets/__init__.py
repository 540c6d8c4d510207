"""What is drawn: plans, details, pictures, as lists of strokes, texts and hatches."""
