"""The wearer: tape measures of one body, how believable they are, and what is peculiar to the figure."""
