"""The words of a series' questions, asking again, and answers told outside the site."""
