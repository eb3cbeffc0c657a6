"""What an answer rests on: its uncertainty, the sources of its figures, its calculation."""
