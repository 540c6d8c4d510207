"""The job file: grammar, frozen models, faults with line and column, JSON Schema, edits."""
