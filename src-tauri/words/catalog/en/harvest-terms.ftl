### Numbers, units and formulas of a harvest.

term =
    .yield = Standing yield
    .price = Price at base moisture
    .base_moisture = Base moisture of the price
    .target_moisture = Own target moisture
    .wettest_to_cut = Highest harvest moisture
    .loss_per_day = Field loss per day
    .loss_below_moisture = Losses begin below
    .loss_per_wet_day = Extra loss on a wet day
    .lodged = Plants lodged
    .lodged_factor = Lodged plants lose, times as fast
    .after_freeze_factor = After a killing freeze all plants lose, times as fast
    .freeze_at_hard_dough = Weight lost to a freeze at hard dough
    .freeze_at_soft_dough = Weight lost to a freeze at soft dough
    .damage_per_wet_day = Damage added by a wet day
    .test_weight_per_wet_day = Test weight lost on a wet day
    .shrink_per_point = Shrink per point
    .drying_charge = Drying charge
    .fuel_price = Fuel price
    .fuel_use = Fuel for drying (as propane)
    .handling = Handling at the dryer
    .dryer_capacity = Dryer capacity per day
    .combine_rate = Combine acres per day
    .cutting_cost = Cutting and hauling
    .test_weight = Test weight
    .heat_damage = Heat-damaged kernels
    .total_damage = Total damage
    .foreign_material = Foreign material
    .broken_and_foreign = Broken kernels and foreign material (BNFM)
    .seeds_per_pound = Seeds by weight
    .seeds_per_head = Seeds on a whole head

unit =
    .percent = %
    .percentADay = % a day
    .percentAPoint = % a point
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
    .centsBuPoint = ¢ per bu and point
    .dollarTPoint = $ per t and point
    .gallonBuPoint = gal per bu and point
    .literTPoint = L per t and point
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
    .sold_shrunk = Sold as cut, shrunk to base moisture
    .sold_by_weight = Sold as cut, by weight
    .dried_first = Dried first in my dryer

outlet-label = Where the grain goes

wet-grain =
    .shrink = Shrink factor
    .table = Discount table
    .energy = Cost of drying

wet-grain-label = How the buyer charges for wet grain

fuel =
    .propane = Propane
    .natural_gas = Natural gas
    .electricity = Electricity

fuel-label = The dryer burns

factor =
    .moisture = Moisture
    .test_weight = Test weight
    .heat_damage = Heat damage
    .total_damage = Total damage
    .foreign_material = Foreign material
    .broken_and_foreign = Broken kernels and foreign material (BNFM)

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
    .assumed = app default

formula =
    .dry_share = Weight at base moisture per weight as cut
    .wet_value = Value of wet grain
    .over_dry_value = Value of grain drier than the base
    .buyer_shrink = Value of wet grain by the buyer’s shrink
    .drying_cost = Fuel to dry a bushel
    .all_energy_cost = Fuel and fans to dry a bushel
    .ground_loss = Loss on the ground

quantity =
    .moisture = moisture
    .base_moisture = base moisture
    .grain_price = price
    .shrink_per_point = shrink per point
    .fuel_price = fuel price
    .fuel_use = fuel per bushel and point
    .dry_share = share
    .value = value
    .cost = cost
    .seeds_on_ground = seeds on the ground
    .seeds_per_pound = seeds per pound
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

not-said = Not set
set-for-all = for all plantings
set-for-this = for this planting

# $what (String)
take-back = Clear my value: { $what }

# $low (String)
# $high (String)
may-lie = could be { $low } to { $high }

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
