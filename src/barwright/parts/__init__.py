"""What can be bought, measured or bolted on: frozen records that hold quantities.

Records hold and type-check; they do not load, compute or judge.
"""
