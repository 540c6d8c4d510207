"""The workspace: the whole job in a browser, on this machine.  It asks `plan` and computes nothing."""
