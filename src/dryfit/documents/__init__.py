"""Papers and files made from a book: display lists, sheets, PDF, tables, book.json, the model."""
