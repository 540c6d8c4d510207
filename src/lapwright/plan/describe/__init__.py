"""A job as it is described: what is typed so far, drawn and told field by field, also where much is missing."""
