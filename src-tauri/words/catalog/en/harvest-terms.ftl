### Numbers, units and formulas of a harvest.

term =
    .yield = Yield that stands
    .price = Price at base moisture
    .base_moisture = Base moisture of the price
    .target_moisture = Own target moisture
    .wettest_to_cut = Wettest grain to cut
    .loss_per_day = Loss by standing
    .loss_below_moisture = Losses begin below
    .loss_per_wet_day = Further loss on a wet day
    .lodged = Plants lodged
    .lodged_factor = A lodged plant loses, times as fast
    .after_freeze_factor = After a killing freeze all lose, times as fast
    .freeze_at_hard_dough = Weight lost to a freeze at hard dough
    .freeze_at_soft_dough = Weight lost to a freeze at soft dough
    .damage_per_wet_day = Damage that a wet day adds
    .test_weight_per_wet_day = Test weight that a wet day takes
    .fuel_price = Price of the fuel
    .fuel_use = Fuel that drying takes (as propane)
    .handling = Handling at the dryer
    .dryer_capacity = What the dryer takes
    .combine_rate = What the combine cuts
    .cutting_cost = Cutting and hauling
    .test_weight = Test weight
    .heat_damage = Heat-damaged kernels
    .total_damage = Damaged kernels, all
    .foreign_material = Foreign material
    .broken_and_foreign = Broken kernels and foreign material
    .seeds_per_pound = Seeds by weight
    .seeds_per_head = Seeds of a whole head

unit =
    .percent = %
    .percentADay = % a day
    .points = points
    .times = ×
    .seeds = seeds
    .busAcre = bu/ac
    .tHectare = t/ha
    .dollarBu = $/bu
    .dollarT = $/t
    .dollarGallon = $/gal
    .dollarLiter = $/L
    .dollarTherm = $/therm
    .dollarKwh = $/kWh
    .gallonBuPoint = gal/bu and point
    .literTPoint = L/t and point
    .buPointsDay = bu × points/day
    .tPointsDay = t × points/day
    .acresDay = ac/day
    .hectaresDay = ha/day
    .dollarAcre = $/ac
    .dollarHectare = $/ha
    .poundsBu = lb/bu
    .kgHl = kg/hL
    .seedsPound = seeds/lb
    .seedsKg = seeds/kg

outlet =
    .sold_shrunk = Sold as cut, shrunk to base
    .sold_by_weight = Sold as cut, by its weight
    .dried_first = Dried first in my dryer

outlet-label = Where the grain goes

fuel =
    .propane = Propane
    .natural_gas = Natural gas
    .electricity = Electricity

fuel-label = The dryer burns

factor =
    .moisture = Moisture
    .test_weight = Test weight
    .heat_damage = Heat damage
    .total_damage = Damage, all
    .foreign_material = Foreign material
    .broken_and_foreign = Broken and foreign

grade =
    .no_1 = U.S. No. 1
    .no_2 = U.S. No. 2
    .no_3 = U.S. No. 3
    .no_4 = U.S. No. 4
    .sample_grade = U.S. Sample grade

meter =
    .hand = Hand meter
    .bench = Bench meter
    .oven = Oven

whose =
    .user = yours
    .counted = counted here
    .published = published
    .assumed = a guess of Headwalk

formula =
    .dry_share = Weight at base moisture per weight as cut
    .wet_value = Value of wet grain
    .over_dry_value = Value of grain drier than the base
    .drying_cost = Fuel to dry a bushel
    .all_energy_cost = Fuel and fans to dry a bushel
    .ground_loss = Loss on the ground

quantity =
    .moisture = moisture
    .base_moisture = base moisture
    .grain_price = price
    .fuel_price = price of fuel
    .fuel_use = fuel for a bushel and a point
    .dry_share = share
    .value = value
    .cost = cost
    .seeds_on_ground = seeds on the ground
    .seeds_per_pound = seeds to a pound
    .loss = loss

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
    .seeds_per_square_foot = seeds/ft²
    .seeds_per_pound = seeds/lb
    .bushels_per_acre = bu/ac

not-said = not said
set-for-all = for all plantings
set-for-this = for this planting

# $what (String)
take-back = Take mine back: { $what }

# $low (String)
# $high (String)
may-lie = may lie between { $low } and { $high }

# $what (String)
# $value (String)
# $whose (String)
change = { $what }: { $value }, { $whose }. Change it

# $what (String)
# $unit (String)
type = { $what }, { $unit }

# $text (String)
source = Source: { $text }.

# $result (Number)
# $unit (String)
result = = { NUMBER($result, maximumFractionDigits: 4) } { $unit }

# $result (Number)
result-alone = = { NUMBER($result, maximumFractionDigits: 4) }
