"""The book: reports turned into a PDF for the workshop and the file.

Look in ``contents`` for what is printed, in ``templates`` for how it looks. The owner's text
reaches the template only as data.
"""
