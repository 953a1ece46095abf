crews-head_none = { $yard }: nobody but this chat. Invite someone who helps, looks after it or just wants to see:
crews-head = { $yard }: shared with
crews-member = { $name }: { $role }, since { $since }
crews-lately = Lately: { $zones }, { $on }, confirmed by { $name }.
crews-role_see = may see
crews-role_confirm = may see and confirm
crews-role_change = may see, confirm and change
crews-somebody = somebody
crews-button_invite_see = Invite to see
crews-button_invite_confirm = Invite to confirm
crews-button_invite_change = Invite to change
crews-button_all_see = To all { $count } yards, to see
crews-button_all_confirm = To all { $count } yards, to confirm
crews-button_all_change = To all { $count } yards, to change
crews-button_remove = Remove { $name }
crews-button_leave = Leave { $yard }
crews-group = In a group chat everyone shares its yards: the group is the crew.
crews-member_view = { $yard } is shared with you: you { $role }. Leave it with the button.
crews-invited_link =
    Send this on to one person; they { $role } { $yard }. It works once, until { $until }:
    { $how }
crews-invited =
    Send this on to one person; they { $role } { $yard }. It works once, until { $until }. They type to me:
    { $how }
crews-joined = { $yard } is shared with you now: you { $role }. /today lists what is to be done, /yard shows it.
crews-joined_all = { $count } yards are shared with you now: you { $role } them; new ones come by themselves. /today lists what is to be done.
crews-own_yard = { $yard } belongs to this chat already. The invitation stays good: send it to somebody else.
crews-no_invitation = I know no such invitation. Ask for a new one: the other person says /crew
crews-used = That invitation has been taken up; each works once. Ask for a new one: /crew
crews-ran_out = That invitation has run out. Ask for a new one: /crew
crews-left = Left: { $yard } is no longer yours to see. To come back you need a new invitation.
crews-removed = { $name } no longer shares { $yard }, from this moment on, old buttons included. Open invitations to it are withdrawn.
crews-gone_already = That is over already.
crews-may_not = { $role ->
    [see] { $yard } is shared with you to see; that is not part of it. Ask its people: /crew
    [confirm] { $yard } is shared with you to see and confirm; that is not part of it. Ask its people: /crew
   *[change] { $yard } is shared with you to see, confirm and change; that is not part of it. Ask its people: /crew
 }
crews-admins_only = In a group that is for its admins: it concerns everybody here. Ask one of them.
