troubles-missing = No soil data for this place yet. Use a thermometer at 2 in until I have some.
troubles-old = CAREFUL: my newest soil data is { SPAN($days) } old.
troubles-out = The weather service has been silent since { $day }. I am using the last data I had.
troubles-back = The weather service is back after silence since { $day }. What I say now is current.
troubles-disagrees_warmer = Two weather sources differ by { $gap } here, and mine is warmer. Check with a thermometer at 2 inches.
troubles-disagrees_cooler = Two weather sources differ by { $gap } here, and mine is cooler. Check with a thermometer at 2 inches.
