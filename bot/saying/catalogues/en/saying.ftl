saying-day_pattern = EEE MMM d
saying-far_day_pattern = EEE MMM d, y
saying-short_day_pattern = MMM d
saying-clock_pattern = h:mm a
saying-hour_pattern = h a
# A day in a sentence: { DAY($day) } alone, { DAY($day, style: "about") } after a preposition and so on. $near is today, yesterday, tomorrow or far.
saying-day_plain = { $near ->
        [today] today
        [yesterday] yesterday
        [tomorrow] tomorrow
       *[far] { $date }
    }
saying-day_about = { $near ->
        [today] today
        [yesterday] yesterday
        [tomorrow] tomorrow
       *[far] about { $date }
    }
saying-day_on = { $near ->
        [today] today
        [yesterday] yesterday
        [tomorrow] tomorrow
       *[far] on { $date }
    }
saying-moment = { $day } { $time }
