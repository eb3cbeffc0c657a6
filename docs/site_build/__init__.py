"""What the build of the site adds to Sphinx, one file for each thing."""
