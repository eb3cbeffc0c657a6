"""The questions that columns can be asked, a file each."""
