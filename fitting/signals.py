"""What fitting tells others, without knowing them."""

from django.dispatch import Signal

yard_changed = Signal()  # sent after the commit; sender: the Yard class; yard: its pk
# Sent inside the write that added or changed a horse; sender: the Horse class; horse.
horse_written = Signal()
