"""The builder's file becomes the model, or an error that says what to write."""

from surfacecheck.reading._read import read, read_text

__all__ = ["read", "read_text"]
