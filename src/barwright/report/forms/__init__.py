"""Answers for programs: JSON, SARIF, JUnit, annotations."""
