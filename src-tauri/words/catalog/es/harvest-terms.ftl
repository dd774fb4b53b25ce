### Numbers, units and formulas of a harvest.

term =
    .yield = Rendimiento en pie
    .price = Precio a humedad base
    .base_moisture = Humedad base del precio
    .target_moisture = Humedad objetivo propia
    .wettest_to_cut = Humedad máxima de cosecha
    .loss_per_day = Pérdida por día en pie
    .loss_below_moisture = Las pérdidas empiezan bajo
    .loss_per_wet_day = Pérdida adicional en un día lluvioso
    .lodged = Plantas acamadas
    .lodged_factor = Una planta acamada pierde, veces más rápido
    .after_freeze_factor = Tras una helada letal todas pierden, veces más rápido
    .freeze_at_hard_dough = Peso perdido por helada en grano pastoso duro
    .freeze_at_soft_dough = Peso perdido por helada en grano pastoso
    .damage_per_wet_day = Daño que suma un día lluvioso
    .test_weight_per_wet_day = Peso hectolítrico que quita un día lluvioso
    .shrink_per_point = Merma por punto
    .drying_charge = Cargo por secado
    .fuel_price = Precio del combustible
    .fuel_use = Combustible para secar (como propano)
    .handling = Manejo en la secadora
    .dryer_capacity = Capacidad de la secadora por día
    .combine_rate = Superficie de cosecha por día
    .cutting_cost = Corte y acarreo
    .test_weight = Peso hectolítrico
    .heat_damage = Granos dañados por calor
    .total_damage = Daño total
    .foreign_material = Material extraño
    .broken_and_foreign = Granos quebrados y material extraño (BNFM)
    .seeds_per_pound = Semillas por peso
    .seeds_per_head = Semillas de una panoja entera

unit =
    .percent = %
    .percentADay = % al día
    .percentAPoint = % por punto
    .points = puntos
    .times = ×
    .seeds = semillas
    .busAcre = bu/ac
    .tHectare = t/ha
    .dollarBu = $/bu
    .dollarT = $/t
    .dollarGallon = $/gal
    .dollarLiter = $/L
    .dollarTherm = $/therm
    .dollarKwh = $/kWh
    .centsBuPoint = ¢/bu y punto
    .dollarTPoint = $/t y punto
    .gallonBuPoint = gal/bu y punto
    .literTPoint = L/t y punto
    .buPointsDay = bu × puntos/día
    .tPointsDay = t × puntos/día
    .acresDay = ac/día
    .hectaresDay = ha/día
    .dollarAcre = $/ac
    .dollarHectare = $/ha
    .poundsBu = lb/bu
    .kgHl = kg/hL
    .seedsPound = semillas/lb
    .seedsKg = semillas/kg

outlet =
    .sold_shrunk = Se vende húmedo, con merma a base
    .sold_by_weight = Se vende húmedo, por su peso
    .dried_first = Se seca antes en mi secadora

outlet-label = Destino del grano

wet-grain =
    .shrink = Factor de merma
    .table = Tabla de descuentos
    .energy = Costo de secado

wet-grain-label = Cómo cobra el comprador el grano húmedo

fuel =
    .propane = Propano
    .natural_gas = Gas natural
    .electricity = Electricidad

fuel-label = La secadora usa

factor =
    .moisture = Humedad
    .test_weight = Peso hectolítrico
    .heat_damage = Daño por calor
    .total_damage = Daño total
    .foreign_material = Material extraño
    .broken_and_foreign = Granos quebrados y material extraño (BNFM)

grade =
    .no_1 = U.S. No. 1
    .no_2 = U.S. No. 2
    .no_3 = U.S. No. 3
    .no_4 = U.S. No. 4
    .sample_grade = U.S. Sample grade (fuera de grado)

meter =
    .hand = Medidor de mano
    .bench = Medidor de mesa
    .oven = Estufa

whose =
    .user = suyo
    .counted = contado aquí
    .published = publicado
    .assumed = valor de la aplicación

formula =
    .dry_share = Peso a humedad base por peso cortado
    .wet_value = Valor del grano húmedo
    .over_dry_value = Valor del grano más seco que la base
    .buyer_shrink = Valor del grano húmedo con la merma del comprador
    .drying_cost = Combustible para secar un bushel
    .all_energy_cost = Combustible y ventiladores para secar un bushel
    .ground_loss = Pérdida en el suelo

quantity =
    .moisture = humedad
    .base_moisture = humedad base
    .grain_price = precio
    .shrink_per_point = merma por punto
    .fuel_price = precio del combustible
    .fuel_use = combustible por bushel y punto
    .dry_share = proporción
    .value = valor
    .cost = costo
    .seeds_on_ground = semillas en el suelo
    .seeds_per_pound = semillas por libra
    .loss = pérdida

formula-unit =
    .percent = %
    .ratio = { "" }
    .dollars_per_cwt = $/cwt
    .dollars_per_bushel = $/bu
    .dollars_per_gallon = $/gal
    .dollars_per_therm = $/therm
    .dollars_per_kilowatt_hour = $/kWh
    .gallons_per_bushel_point = gal
    .therms_per_bushel_point = therm
    .kilowatt_hours_per_bushel_point = kWh
    .seeds_per_square_foot = semillas/pie²
    .seeds_per_pound = semillas/lb
    .bushels_per_acre = bu/ac

not-said = Sin indicar
set-for-all = para todas las siembras
set-for-this = para esta siembra
take-back = Borrar mi valor: { $what }
may-lie = puede ser de { $low } a { $high }
change = { $what }: { $value }, { $whose }. Cambiarlo
type = { $what }, { $unit }
source = Fuente: { $text }.
result = = { NUMBER($result, maximumFractionDigits: 4) } { $unit }
result-alone = = { NUMBER($result, maximumFractionDigits: 4) }
