"""What fitting tells others, without knowing them."""

from django.dispatch import Signal

yard_changed = Signal()  # sent after the commit; sender: the Yard class; yard: its pk
# Sent inside the write that added or changed a horse; sender: the Horse class; horse.
horse_written = Signal()
# Sent inside the write of a try-on whose stop sign asks for the vet; sender: the TryOn
# class; tryon. What holds the horse's work listens.
vet_wanted = Signal()
# Asked where one horse's try-ons are read; sender: the Horse class; horse. A receiver
# returns what else was seen of tack on the horse, as a tuple of try-ons.
tryons_asked = Signal()
# Asked where the try-ons of a whole yard are read; sender: the Yard class; yard. A
# receiver returns them as lists by the horse's pk.
yard_tryons_asked = Signal()
# Asked where it is told what a horse has worn; sender: the Horse class; horse. A
# receiver returns what else says so, as a tuple of ``fitting.wearing.Wore``.
worn_asked = Signal()
# Asked where a sign to ring the vet is shown; sender: the Yard class; yard. A receiver
# returns by the horse's pk from when it is off work, and its first day back, if known.
off_work_asked = Signal()
# Asked before an item or a made-up set is deleted; sender: the Tack or the TackSet
# class; thing. A receiver returns what else hangs on it, as a tuple of
# ``fitting.hangs_on.HangsOn``.
records_asked = Signal()
