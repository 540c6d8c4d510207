"""The command line: asks plan, computes nothing."""
