"""How a whole vehicle stands on its four wheels, and which turns of the nuts balance it."""
