def check_book(book): pass
