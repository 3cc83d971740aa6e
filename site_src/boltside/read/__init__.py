"""Reads pattern folders into `boltside.pattern` models, or says everything that is wrong with them.

From the outside in: `text_file` (safe reading) → `yaml_tree`, `svg_tree`, `body_chart`, `steps` (text with places) →
`document` (the file as types), `svg_file` (shapes in mm) → `outline` (one piece and size) → checks → `make` (models).
`folder` is the door.
"""
