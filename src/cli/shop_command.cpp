#include "cli/shop_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/shop_show.h"

namespace coatwright {
namespace {

/// The options of `shop set`, as typed; empty: not given.
struct SetOptions {
  std::string usual_day;
  std::string hours;
  std::string time_zone;
  std::string units;
  std::string people;
  std::string spray_places;
  std::string rack_places;
  std::string benches;
  std::string finishing_room;
  std::string learned_recoat;
  std::string room;
  std::string fan;
  std::string fan_rated;
  std::string mixing;
  std::string ignition;
  std::string emergency;
  std::string cabinet;
  std::vector<std::string> closed;
  std::vector<std::string> open;
  std::vector<std::string> usual;
};

/// What a call changes.
struct Changes {
  std::map<ShopSetting, std::string> values;
  DayChanges days;
};

/// Adds one given option to what is to be stored, once its parser has read it.
/// @param option named in its error; empty: the parser names it.
template <class Parse>
Result<void> take(const std::string& option,
                  const std::string& text,
                  ShopSetting which,
                  Parse parse,
                  std::map<ShopSetting, std::string>& into) {
  if (text.empty()) {
    return {};
  }
  if (const auto value = parse(text); !value) {
    return option.empty() ? pass_on(value.error()) : pass_on(value.error(), option);
  }
  into[which] = text;
  return {};
}

Result<std::map<ShopSetting, std::string>> checked_values(const SetOptions& options) {
  std::map<ShopSetting, std::string> values;
  const Result<void> results[] = {
      take("", options.usual_day, ShopSetting::kUsualDay, UsualDay::parse, values),
      take("", options.hours, ShopSetting::kHours, WeekHours::parse, values),
      take("", options.time_zone, ShopSetting::kTimeZone, Zone::find, values),
      take("", options.units, ShopSetting::kUnits, parse_units, values),
      take("--people", options.people, ShopSetting::kPeople, WeekPeople::parse, values),
      take("--spray-places", options.spray_places, ShopSetting::kSprayPlaces, parse_places, values),
      take("--rack-places", options.rack_places, ShopSetting::kRackPlaces, parse_places, values),
      take("--benches", options.benches, ShopSetting::kBenches, parse_places, values),
      take("--finishing-room",
           options.finishing_room,
           ShopSetting::kFinishingRoom,
           parse_finishing_room,
           values),
      take("--learned-recoat",
           options.learned_recoat,
           ShopSetting::kLearnedRecoat,
           parse_learned_recoat,
           values),
      take("--room", options.room, ShopSetting::kRoom, parse_room_setting, values),
      take("--fan", options.fan, ShopSetting::kFan, parse_fan_setting, values),
      take("--fan-rated", options.fan_rated, ShopSetting::kFanRated, parse_fan_rating, values),
      take("--mixing", options.mixing, ShopSetting::kMixing, parse_mixing, values),
      take("--ignition", options.ignition, ShopSetting::kIgnition, parse_words, values),
      take("--emergency", options.emergency, ShopSetting::kEmergency, parse_words, values),
      take("--cabinet", options.cabinet, ShopSetting::kCabinet, parse_yes_or_no, values)};
  for (const auto& result : results) {
    if (!result) {
      return pass_on(result.error());
    }
  }
  return values;
}

/// Adds what becomes of one day. Errors: kUsage when the call speaks of it twice.
Result<void> add_day(date::local_days day,
                     const std::optional<SpecialDay>& special,
                     DayChanges& days) {
  if (!days.emplace(day, special).second) {
    return fail(ErrorCode::kUsage,
                fmt::format("{} is there twice; say one thing of a day", date_text(day)));
  }
  return {};
}

/// Adds days that are all closed, or all as usual again.
Result<void> add_ranges(const std::string& option,
                        const std::vector<std::string>& texts,
                        const std::optional<SpecialDay>& special,
                        DayChanges& days) {
  for (const std::string& text : texts) {
    const auto range = parse_day_range(text);
    if (!range) {
      return pass_on(range.error(), option);
    }
    for (auto day = range->first; day <= range->last; day += date::days(1)) {
      if (const auto added = add_day(day, special, days); !added) {
        return pass_on(added.error(), option);
      }
    }
  }
  return {};
}

Result<DayChanges> checked_days(const SetOptions& options) {
  DayChanges days;
  if (const auto added = add_ranges("--closed", options.closed, SpecialDay{}, days); !added) {
    return pass_on(added.error());
  }
  if (const auto added = add_ranges("--usual", options.usual, std::nullopt, days); !added) {
    return pass_on(added.error());
  }
  for (const std::string& text : options.open) {
    const auto dated = parse_open_day(text);
    if (!dated) {
      return pass_on(dated.error(), "--open");
    }
    if (const auto added = add_day(dated->day, dated->special, days); !added) {
      return pass_on(added.error(), "--open");
    }
  }
  return days;
}

Result<Changes> checked(const SetOptions& options) {
  auto values = checked_values(options);
  if (!values) {
    return pass_on(values.error());
  }
  auto days = checked_days(options);
  if (!days) {
    return pass_on(days.error());
  }
  if (values->empty() && days->empty()) {
    return fail(ErrorCode::kUsage,
                "shop set needs at least one of its options, such as --usual-day, --hours or "
                "--people");
  }
  return Changes{std::move(*values), std::move(*days)};
}

Result<ExitCode> run_set(const SetOptions& options, const GlobalOptions& global) {
  const auto changes = checked(options);
  if (!changes) {
    return pass_on(changes.error());
  }
  auto session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.set(changes->values, changes->days); !done) {
    return pass_on(done.error());
  }
  return run_shop_show(global);
}

}  // namespace

void add_shop(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& shop = add_group(app, "shop", "What plans need to know of the shop");
  CLI::App* set = shop.add_subcommand("set", "Change settings");
  auto options = std::make_shared<SetOptions>();
  const auto option = [set](const char* name, auto& value, const char* type, const char* about) {
    set->add_option(name, value, about)->type_name(type);
  };
  option("--usual-day",
         options->usual_day,
         "POINTS",
         "Air on the clock: \"7:00 19C 50%; 22:00 15C 60%\"");
  option("--hours", options->hours, "HOURS", "When people work: \"Mon-Fri 8:00-17:00\"");
  option(
      "--people", options->people, "PEOPLE", "How many are there: \"3; Fri 2; Sat 9:00-13:00 1\"");
  option("--spray-places", options->spray_places, "COUNT", "Where one can spray at a time; or any");
  option("--rack-places", options->rack_places, "COUNT", "Of the drying rack; or any");
  option("--benches", options->benches, "COUNT", "To work at; or any");
  option("--finishing-room",
         options->finishing_room,
         "apart|shared",
         "Where films dry: apart from the benches' dust, or not");
  option("--learned-recoat",
         options->learned_recoat,
         "not-below-label|as-tested",
         "Whether touch tests may open a recoat before the label's shortest time");
  option("--room",
         options->room,
         "SIZE|none",
         "Length x width x height where films dry: 6x5x3m or 20x16x10ft");
  option("--fan", options->fan, "FLOW|none", "What its exhaust fan moves: 850m3/h or 500cfm");
  option("--fan-rated",
         options->fan_rated,
         "yes|no|unknown",
         "Whether fan and motor are rated for flammable vapour");
  option("--mixing", options->mixing, "K", "How badly its air mixes: 1 (perfect) to 10 (poor)");
  option("--ignition",
         options->ignition,
         "WORDS|none",
         "What could ignite vapour in it: \"pilot light, unrated fan motor\"");
  option("--emergency",
         options->emergency,
         "WORDS|none",
         "Whom to call, for the safety sheet: \"fire 911; poison centre ...\"");
  option("--cabinet",
         options->cabinet,
         "yes|no",
         "Whether flammable liquids stand in a cabinet made for them");
  option("--closed", options->closed, "DAYS", "A day, 2027-05-01, or days, 2027-12-24..2028-01-02");
  option("--open",
         options->open,
         "DAY",
         "Hours of one day: \"2027-05-08 9:00-13:00\", with people: \"... 2\"");
  option("--usual", options->usual, "DAYS", "Takes days back to the usual hours");
  option("--time-zone", options->time_zone, "AREA/CITY", "The shop's IANA time zone");
  option("--units", options->units, "SYSTEM", "How quantities are shown: metric or us");
  set->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_set(*options, global); }; });
  CLI::App* show = shop.add_subcommand("show", "Show the settings, and which are defaults");
  show->callback([&global, &chosen] { chosen = [&global] { return run_shop_show(global); }; });
}

}  // namespace coatwright
