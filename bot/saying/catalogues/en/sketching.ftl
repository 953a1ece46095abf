sketching-none = Nothing to draw yet. Tell me a zone: front 60x40 ft, or walk its corners: walk front
sketching-button_photo = My photo
sketching-photo_kept =
    Kept with { $yard }: your photo. Say "my photo" to see it again.
    I can't read sizes from it; tell me in words: front 60x40 ft
sketching-photo = { $yard }, your photo of { $day }.
sketching-photo_none = No photo kept with { $yard }. Send one of your sketch on paper, and I keep it here.
sketching-photo_gone = Your photo of { $day } is no longer where it was kept. Please send it again.
sketching-down = down already
sketching-late = too late there
sketching-photo_of_label =
    Kept with { $yard }. I take no dose from a photo: type what the label says, one figure after the other.
    Front: active ingredient and percentage, net weight. Back: what it covers, and "do not apply more than".
