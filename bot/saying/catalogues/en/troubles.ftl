troubles-missing = No soil data for this place so far. Go by a thermometer at 2 in until I have some.
troubles-old = CAREFUL: the newest measured day is { SPAN($days) } old.
troubles-out = The weather service has not answered since { $day }; what I say stands on what I had.
troubles-back = The weather service is back; it had been silent since { $day }. What I say now is fresh again.
troubles-disagrees_warmer = Two sources disagree by { $gap } here; mine is the warmer. Check with a thermometer at 2 in.
troubles-disagrees_cooler = Two sources disagree by { $gap } here; mine is the cooler. Check with a thermometer at 2 in.
