"""The addresses of the workspace, a module for each kind."""
