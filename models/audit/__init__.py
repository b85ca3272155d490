"""One rule, one sentence, wherever a plan comes from; what is asked is flagged until answered."""
