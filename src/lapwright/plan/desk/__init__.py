"""What a person does to a job at the desk, as values: the same from a page, a script or a file."""
