"""The names by which a project is found, before any record is read."""

from __future__ import annotations

FOLDER = "as-built"
PROJECT_FILE = "project.md"
PRINTED = "job-sheets"
"""The folder of pages for the printer below `as-built/`; git passes it over."""
