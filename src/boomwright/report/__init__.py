"""What there is to say of each subject: facts, tables, pictures and notices, a folder each."""
