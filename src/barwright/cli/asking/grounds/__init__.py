"""Commands that show what an answer rests on."""
