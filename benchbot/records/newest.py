"""The newest migration of the record, known without loading the tools that apply it."""

from __future__ import annotations

NEWEST = "0004"
