#include "air/logger_heading.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <initializer_list>

namespace coatwright {
namespace {

using Words = std::vector<std::string>;

struct Letter {
  std::string_view from;
  std::string_view to;
};

// A full stop vanishes, so that "Temp.", "r.F." and "temp" are plain words.
constexpr std::array<Letter, 13> kLetters = {{{"é", "e"},
                                              {"É", "e"},
                                              {"è", "e"},
                                              {"ê", "e"},
                                              {"ü", "u"},
                                              {"ä", "a"},
                                              {"ö", "o"},
                                              {"ß", "ss"},
                                              {"℃", " c "},
                                              {"℉", " f "},
                                              {"%", " % "},
                                              {".", ""},
                                              {"°", " "}}};

std::string plain(std::string_view heading) {
  std::string text;
  while (!heading.empty()) {
    const auto letter = std::find_if(kLetters.begin(), kLetters.end(), [&](const Letter& one) {
      return heading.substr(0, one.from.size()) == one.from;
    });
    if (letter != kLetters.end()) {
      text += letter->to;
      heading.remove_prefix(letter->from.size());
      continue;
    }
    const auto c = static_cast<unsigned char>(heading.front());
    text += std::isalnum(c) != 0 ? static_cast<char>(std::tolower(c)) : ' ';
    heading.remove_prefix(1);
  }
  return text;
}

Words words_of(std::string_view heading) {
  Words words(1);
  for (const char c : plain(heading)) {
    if (c != ' ') {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) {
    words.pop_back();
  }
  return words;
}

bool has_word(const Words& words, std::initializer_list<std::string_view> wanted) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::find(wanted.begin(), wanted.end(), word) != wanted.end();
  });
}

bool has_part(const Words& words, std::initializer_list<std::string_view> wanted) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::any_of(wanted.begin(), wanted.end(), [&](std::string_view part) {
      return word.find(part) != std::string::npos;
    });
  });
}

/// Figures that are neither the air's temperature nor its relative humidity, though named like
/// them.
bool is_another_figure(const Words& words) {
  return has_part(words,
                  {"dew",         "taupunkt",   "rosee",       "frost",      "bulb",
                   "feuchtkugel", "feuchttemp", "feuchtetemp", "holzfeucht", "materialfeucht",
                   "chill",       "index",      "apparent",    "ressenti",   "gefuhlt",
                   "feels",       "absolut",    "specific",    "spezifisch", "ratio",
                   "mixing",      "mischung",   "setpoint",    "alarm",      "batter",
                   "soil",        "surface",    "deficit",     "defizit",    "pressure"}) ||
         has_word(words,
                  {"wet",
                   "mouillee",
                   "humide",
                   "min",
                   "max",
                   "low",
                   "high",
                   "set",
                   "soll",
                   "consigne",
                   "abs",
                   "sd",
                   "std",
                   "stdev",
                   "ah"});
}

bool is_celsius(const Words& words) {
  return has_word(words, {"c", "celsius", "degc", "gradc", "tempc", "temperaturec"});
}

bool is_fahrenheit(const Words& words) {
  return has_word(words, {"f", "fahrenheit", "degf", "gradf", "tempf", "temperaturef"});
}

bool names_temperature(const Words& words, std::string_view heading) {
  const bool named = has_part(words, {"temperatur"}) ||
                     has_word(words, {"celsius", "fahrenheit"}) ||
                     std::any_of(words.begin(), words.end(), [](const std::string& word) {
                       return word.substr(0, 4) == "temp";
                     });
  const bool has_unit = is_celsius(words) || is_fahrenheit(words);
  const bool unit_alone =
      words.size() == 1 && has_unit && heading.find("°") != std::string_view::npos;
  return named || unit_alone || (has_unit && has_word(words, {"t"}));
}

bool names_humidity(const Words& words) {
  const bool numbered = std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return word.size() == 3 && word.substr(0, 2) == "rh" &&
           std::isdigit(static_cast<unsigned char>(word[2])) != 0;
  });
  // "hr" is humidité relative, or an hour: the sign must tell.
  return numbered || has_part(words, {"humid", "feucht", "relhum"}) ||
         has_word(words, {"rh", "rf", "hum", "humi", "relh"}) ||
         (has_word(words, {"hr"}) && has_word(words, {"%"}));
}

CellUnit unit_in(const Words& words) {
  if (is_celsius(words) != is_fahrenheit(words)) {
    return is_celsius(words) ? CellUnit::kCelsius : CellUnit::kFahrenheit;
  }
  return has_word(words, {"%", "percent", "pct", "prozent", "pourcent"}) ? CellUnit::kPercent
                                                                         : CellUnit::kNone;
}

bool says_fraction(const Words& words, std::string_view heading) {
  const auto has = [&](std::string_view part) {
    return heading.find(part) != std::string_view::npos;
  };
  return has_word(words, {"fraction", "anteil", "bruchteil"}) || has("0-1)") || has("0..1)");
}

}  // namespace

HeadingMeaning meaning_of_heading(std::string_view heading) {
  const Words words = words_of(heading);
  HeadingMeaning meaning;
  const bool stamp = has_word(words,
                              {"timestamp",
                               "datetime",
                               "zeitstempel",
                               "zeitpunkt",
                               "horodatage",
                               "dateheure",
                               "datumzeit",
                               "datumuhrzeit"});
  const bool other_time = has_word(
      words,
      {"zone", "timezone", "elapsed", "interval", "duration", "dauer", "duree", "since", "seit"});
  meaning.date = !other_time && (stamp || has_word(words, {"date", "datum", "jour", "tag"}));
  meaning.clock =
      !other_time && (stamp || has_word(words, {"time", "uhrzeit", "zeit", "heure", "clock"}));
  meaning.temperature = names_temperature(words, heading) && !is_another_figure(words);
  meaning.humidity = names_humidity(words) && !is_another_figure(words);
  if (meaning.temperature && meaning.humidity) {
    meaning.temperature = meaning.humidity = false;
  }
  if (meaning.temperature || meaning.humidity) {
    meaning.date = meaning.clock = false;
  }
  meaning.unit = unit_in(words);
  meaning.fraction = meaning.humidity && says_fraction(words, heading);
  return meaning;
}

std::string heading_without_unit(std::string_view heading) {
  std::string rest;
  for (const std::string& word : words_of(heading)) {
    if (!has_word({word}, {"c", "f", "celsius", "fahrenheit", "degc", "degf", "deg"})) {
      rest += word + " ";
    }
  }
  return rest;
}

}  // namespace coatwright
