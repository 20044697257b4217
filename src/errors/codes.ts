/** Every code of a problem, with what it means: the list that the docs print. A test finds codes that are missing. */
export const CODES = {
  // The text of a file.
  "file-missing": "there is no such file",
  "file-not-regular": "the path is a directory or a device",
  "file-unreadable": "the file can't be opened or read",
  "file-exists": "the output file is there already and would be overwritten",
  "file-too-large": "the file is larger than any study or data file needs to be",
  "file-empty": "the file holds no value",
  "file-encoding": "the file isn't UTF-8 text",
  "yaml-syntax": "the text isn't valid YAML",
  "yaml-alias": "anchors, aliases and merge keys aren't used in these files",
  "yaml-tag": "tags aren't used in these files",
  "yaml-documents": "a file holds one YAML document",
  "yaml-tab": "a tab stands where YAML wants spaces",
  "yaml-depth": "the value is nested too deep",
  "yaml-key": "a key is no plain text",
  "duplicate-key": "a key stands twice in one mapping",
  // The shape of a file.
  "unknown-key": "a key isn't known here",
  "missing-key": "a needed key is absent",
  "wrong-kind": "a value is of the wrong kind, such as a list where text is needed",
  "unknown-word": "a word isn't one of the allowed ones",
  "unknown-format": "the `format` of a data file isn't known",
  "bad-name": "a name holds other than letters, digits, `-` and `_`",
  "too-many-problems": "the list of problems was cut",
  // Figures.
  "bad-number": "a text doesn't begin with a number",
  "unit-missing": "a number has no unit where one is needed",
  "unknown-unit": "a unit isn't known",
  "bad-unit": "a unit text can't be read",
  "wrong-dimension": "a quantity is of another dimension than needed",
  "number-out-of-range": "a number is infinite, or too large or small to compute with",
  "not-whole": "a whole number is needed",
  "out-of-range": "a figure lies outside of what is allowed or possible",
  "bad-spread": "low, value, high, sigma or samples don't make a distribution",
  // Physics and structure of a study.
  "off-below-on": "the off resistance isn't above the on resistance",
  "word-too-wide": "a word doesn't fit a row or the macro",
  "supply-below-threshold": "the supply isn't above the threshold voltage",
  "decks-with-transistor": "cells with a transistor in each can't be stacked",
  "conflicting-keys": "two keys exclude each other",
  "unknown-design": "a name isn't one of the study's designs",
} as const satisfies Record<string, string>;

export type Code = keyof typeof CODES;
