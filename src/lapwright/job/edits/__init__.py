"""Edits of a job file's text: one thing changes, comments and every other character stay."""
