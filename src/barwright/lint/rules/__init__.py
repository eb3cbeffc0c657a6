"""The rules, one a file; :mod:`barwright.lint.catalogue` lists them."""
