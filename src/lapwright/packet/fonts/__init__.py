"""The fonts of the packet, each with its licence, and the widths of their letters."""
