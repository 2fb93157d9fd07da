"""The cabinet sheet: what one place holds and how to make it safe, to be laminated and hung there."""
