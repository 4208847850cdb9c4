"""What is written as a length, a sum or a place, understood: words, grammar, kinds, arithmetic.

Apart because it knows nothing of furniture: names are looked up by whoever asks.
"""
