"""What stands on the pages of the packet, as plain texts; the templates beside decide how it looks."""
