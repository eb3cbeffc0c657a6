"""How a pack is written: its words and kinds of record, its versions, what it asks of barwright."""
