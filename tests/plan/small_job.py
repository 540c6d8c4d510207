"""A job that is planned in a moment: one area of 30' by 12', two plies, no weather."""

# what every roof of these tests is built of
REST = """\
assembly:
  plies:
    - {ply: base, sheet: b}
    - {ply: cap, sheet: c}
sheets:
  b: {width: 39 3/8", length: 65' 7", side_lap: 3", end_lap: 6"}
  c: {width: 39 3/8", length: 32' 10", side_lap: 3", end_lap: 6"}
"""
JOB = (
    """\
job: {name: Small}
units: us
roof:
  - area: Main
    outline: E 30', N 12', W 30', S 12'
    falls: S
    slope: 1/4 in 12
    edges:
      - {sides: 1-4, kind: parapet, height: 30"}
"""
    + REST
)
