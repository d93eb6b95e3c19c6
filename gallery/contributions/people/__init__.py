"""People in the pictures: who is in them, who must agree, and what is cleared for use."""
