saying-day_pattern = EEE d 'de' MMMM
saying-far_day_pattern = EEE d 'de' MMMM 'de' y
saying-short_day_pattern = d MMM
saying-clock_pattern = h:mm a
saying-hour_pattern = h a
saying-day_plain = { $near ->
        [today] hoy
        [yesterday] ayer
        [tomorrow] mañana
       *[far] { $date }
    }
saying-day_about = { $near ->
        [today] hoy
        [yesterday] ayer
        [tomorrow] mañana
       *[far] hacia el { $date }
    }
saying-day_on = { $near ->
        [today] hoy
        [yesterday] ayer
        [tomorrow] mañana
       *[far] el { $date }
    }
saying-moment = { $day }, { $time }
saying-day_from = { $near ->
        [today] de hoy
        [yesterday] de ayer
        [tomorrow] de mañana
       *[far] del { $date }
    }
saying-day_to = { $near ->
        [today] a hoy
        [yesterday] a ayer
        [tomorrow] a mañana
       *[far] al { $date }
    }
