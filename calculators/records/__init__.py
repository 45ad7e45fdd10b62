"""The batch record: entries of a day-book, read, checked, merged, fitted and looked back on."""
