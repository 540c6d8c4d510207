"""Every length and piece that is not a field piece: strips, flashings, corners, drains, pipes, cant and metal."""
