sketching-none = Nothing to draw yet. Tell me a zone: front 60x40 ft, or walk its corners: walk front
sketching-button_photo = My photo
sketching-photo_kept = Saved your photo with { $yard }. Say "my photo" to see it again.
    I can't read sizes from it, so type them: front 60x40 ft
sketching-photo = { $yard }, your photo of { $day }.
sketching-photo_none = No photo saved with { $yard }. Send one of your sketch on paper, and I keep it here.
sketching-photo_gone = Your photo of { $day } is no longer where I saved it. Please send it again.
sketching-down = done
sketching-late = too late
sketching-photo_of_label = Saved with { $yard }. I take no dose from a photo: type what the label says, one figure at a time.
    Front: active ingredient and percent, net weight. Back: what it covers, and "do not apply more than".
sketching-photo_unsure = Saved with { $yard }. I could not read this photo surely enough to go by it. Type what the label says, one figure at a time.
    Front: active ingredient and percent, net weight. Back: what it covers, and "do not apply more than".
sketching-seen_ask_first = Saved. I read the photo, and a photo misleads: check each figure against the label.
    { sketching-seen_ask_next }
sketching-seen_ask_next = { $kind ->
    [ingredient] Active ingredient: { $said }. Does the label say that?
    [strength] Percentage beside it: { $said }. Does the label say that?
    [weight] Net weight: { $said }. Does the label say that?
    [covers] It covers { $said }. Does the label say that?
   *[maximum] { $period ->
        [application] The most it allows: { $said } each time. Does the label say that?
        [season] The most it allows: { $said } in a season. Does the label say that?
       *[year] The most it allows: { $said } in a year. Does the label say that?
    }
}
sketching-button_seen = The label says so
sketching-button_unseen = No, leave it out
sketching-button_label = Photo of the label
sketching-label = The label
