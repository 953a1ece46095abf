crews-head_none = { $yard }: nadie más que este chat. Invita a quien ayude, a quien la cuide o a quien solo quiera ver:
crews-head = { $yard }: compartida con
crews-member = { $name }: puede { $role }, desde { DAY($since, style: "on") }
crews-lately = Lo último: { $zones }, { DAY($on) }, confirmado por { $name }.
crews-role_see = ver
crews-role_confirm = ver y confirmar
crews-role_change = ver, confirmar y cambiar
crews-button_invite_see = Invitar a ver
crews-button_invite_confirm = Invitar a confirmar
crews-button_invite_change = Invitar a cambiar
crews-button_all_see = A las { $count } propiedades, para ver
crews-button_all_confirm = A las { $count } propiedades, para confirmar
crews-button_all_change = A las { $count } propiedades, para cambiar
crews-button_remove = Quitar a { $name }
crews-button_leave = Dejar { $yard }
crews-group = En un chat de grupo todos comparten sus propiedades: el grupo es el equipo.
crews-member_view = { $yard } está compartida contigo: puedes { $role }. Déjala con el botón.
crews-invited_link =
    Reenvía esto a una sola persona; podrá { $role } en { $yard }. Sirve una vez, hasta { DAY($until, style: "on") }:
    { $how }
crews-invited =
    Reenvía esto a una sola persona; podrá { $role } en { $yard }. Sirve una vez, hasta { DAY($until, style: "on") }. Que me escriba:
    { $how }
crews-joined = { $yard } ya está compartida contigo: puedes { $role }. /today da lo que hay que hacer, /yard la muestra.
crews-joined_all = { $count } propiedades ya están compartidas contigo: puedes { $role }; las nuevas se agregan solas. /today da lo que hay que hacer.
crews-own_yard = { $yard } ya es de este chat. La invitación sigue valiendo: mándasela a otra persona.
crews-no_invitation = No conozco esa invitación. Pide otra: la otra persona dice /crew
crews-used = Esa invitación ya se usó; cada una sirve una vez. Pide otra: /crew
crews-ran_out = Esa invitación ya venció. Pide otra: /crew
crews-left = Dejaste { $yard }: ya no la puedes ver. Para volver necesitas otra invitación.
crews-removed = { $name } ya no comparte { $yard }, desde este momento, ni con botones viejos. Las invitaciones abiertas quedan anuladas.
crews-gone_already = Eso ya se acabó.
crews-may_not = { $role ->
    [see] { $yard } está compartida contigo solo para ver; esto no entra. Pregunta a su gente: /crew
    [confirm] { $yard } está compartida contigo solo para ver y confirmar; esto no entra. Pregunta a su gente: /crew
   *[change] { $yard } está compartida contigo solo para ver, confirmar y cambiar; esto no entra. Pregunta a su gente: /crew
 }
crews-admins_only = En un grupo eso es cosa de sus administradores: les toca a todos aquí. Pídeselo a uno de ellos.
crews-all_of_them = todas tus propiedades
