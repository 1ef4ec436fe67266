"""A job whose module takes longer to load than anybody waits: the solver on a bad day."""

import time

time.sleep(60)
