"""The one place where rooms meet."""
