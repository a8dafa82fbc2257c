"""The builder's file becomes the model, or an error that says what to write."""

from surfacecheck.reading._names import edges_and_holes
from surfacecheck.reading._new import starting_file, write_new
from surfacecheck.reading._questions import Question, questions
from surfacecheck.reading._read import read, read_text
from surfacecheck.reading._schema import change_schema, schema_text, study_schema, surface_schema
from surfacecheck.reading._study import StudyFile, read_study
from surfacecheck.reading._values import bracket_of, source_of
from surfacecheck.reading._whole import write_whole

__all__ = [
    "Question",
    "StudyFile",
    "bracket_of",
    "change_schema",
    "edges_and_holes",
    "questions",
    "read",
    "read_study",
    "read_text",
    "schema_text",
    "source_of",
    "starting_file",
    "study_schema",
    "surface_schema",
    "write_new",
    "write_whole",
]
