"""A class typed in plain words, as one would write it on paper, becomes a class wish.

`entry.quick_entry` reads; `written_words.class_in_words` writes a wish in the words that
reading takes back. Nothing is guessed: what is not plain is asked, with the nearest names.
"""
