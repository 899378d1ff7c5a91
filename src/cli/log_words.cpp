#include "cli/log_words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "air/moist_air.h"
#include "base/quantity_text.h"
#include "report/plan_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

constexpr std::size_t kIndent = 5;

/// " on the front of the top", or nothing for the whole piece.
std::string place_of(const LogEntry& entry) {
  const std::string face = entry.face.empty()     ? ""
                           : entry.face == "both" ? "both faces"
                                                  : "the " + entry.face;
  if (face.empty()) {
    return entry.part.empty() ? "" : " on the " + entry.part;
  }
  return " on " + face + (entry.part.empty() ? "" : " of the " + entry.part);
}

/// Where the window lies, of a coat that has one.
std::string window_words(const LoggedFinding& finding, const Zone& zone) {
  if (!finding.moment) {
    return "";
  }
  return fmt::format(" The window {} {}.",
                     finding.kind == "early"  ? "opens"
                     : finding.kind == "late" ? "closed"
                                              : "closes",
                     show_full(*finding.moment, zone));
}

std::string finding_as_text(const LoggedFinding& finding,
                            const Session& session,
                            std::size_t indent) {
  const std::size_t further = indent + 2;
  std::string text = wrap(fmt::format("{}: {}{}",
                                      verdict_head(finding),
                                      as_sentence(finding.text),
                                      window_words(finding, session.zone)),
                          indent,
                          further);
  if (!finding.may_happen.empty()) {
    text += wrap("May happen: " + finding.may_happen, further, further + 2);
  }
  if (!finding.to_do.empty()) {
    text += wrap("To do: " + finding.to_do, further, further + 2);
  }
  return text;
}

/// "revision 85944171f73967e8; 0.20 L; batch 7; by Ines", of what is known.
std::string particulars_of(const LogEntry& entry, UnitSystem units) {
  std::string text;
  const auto add = [&text](const std::string& words) {
    text += (text.empty() ? "" : "; ") + words;
  };
  if (!entry.revision.empty()) {
    add("revision " + entry.revision);
  }
  if (entry.amount) {
    add(show_volume(*entry.amount, units));
  }
  if (!entry.batch.empty()) {
    add("batch " + entry.batch);
  }
  if (entry.abraded) {
    add("abraded before");
  }
  if (!entry.by.empty()) {
    add("by " + entry.by);
  }
  if (!entry.photo.empty()) {
    add("photo " + entry.photo);
  }
  return text;
}

/// What was done or found, without where.
std::string what_of(const LogEntry& entry) {
  if (entry.touch) {
    return fmt::format("touch test '{}'", entry.touch->words);
  }
  if (entry.moisture) {
    return "wood moisture " + moisture_text(*entry.moisture);
  }
  if (!entry.outcome.empty()) {
    return fmt::format("outcome '{}'", entry.outcome);
  }
  return entry.step == "apply" ? "coat of " + entry.product : entry.step;
}

nlohmann::ordered_json text_or_null(const std::string& text) {
  return text.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(text);
}

nlohmann::ordered_json finding_as_json(const LoggedFinding& finding, const Zone& zone) {
  nlohmann::ordered_json whole = {{"kind", finding.kind},
                                  {"by_seconds", finding.by.count()},
                                  {"moment", nullptr},
                                  {"chance", nullptr},
                                  {"text", finding.text},
                                  {"may_happen", text_or_null(finding.may_happen)},
                                  {"to_do", text_or_null(finding.to_do)},
                                  {"source", text_or_null(finding.source)}};
  if (finding.moment) {
    whole["moment"] = show_rfc3339(*finding.moment, zone);
  }
  if (finding.chance) {
    whole["chance"] = rounded(*finding.chance, 3);
  }
  return whole;
}

nlohmann::ordered_json air_as_json(const LoggedAir& air) {
  return {{"temp_c", rounded(air.temperature.celsius(), 2)},
          {"rh_percent", rounded(air.humidity.percent(), 1)},
          {"dew_point_c", rounded(dew_point(air.temperature, air.humidity).celsius(), 2)},
          {"from", name_of(air.origin)}};
}

}  // namespace

std::string deed_of(const LogEntry& entry) {
  std::string deed = what_of(entry);
  if (!entry.grit.empty()) {
    deed += " " + entry.grit;
  }
  deed += place_of(entry);
  return entry.kind == LogKind::kSkip ? deed + " left out" : deed;
}

std::string touch_words(const LoggedTouch& touch) {
  return fmt::format("{}: {}", name_of(touch.stage), touch.reached ? "reached" : "not reached yet");
}

std::string moisture_text(double fraction) {
  return fmt::format("{:.1f} %", 100.0 * fraction);
}

std::string logged_line(const LogEntry& entry, const Session& session) {
  return wrap(fmt::format("Logged entry {} for {}: {}, {}.",
                          entry.id,
                          entry.piece,
                          deed_of(entry),
                          show_full(entry.at, session.zone)),
              0,
              2);
}

std::string verdict_head(const LoggedFinding& finding) {
  return finding.by.count() == 0 ? finding.kind : finding.kind + " by " + show_duration(finding.by);
}

std::string air_words(const LoggedAir& air, UnitSystem units) {
  return fmt::format("{}, {}, dew point {} ({})",
                     temperature_text(air.temperature, units),
                     show_humidity(air.humidity),
                     temperature_text(dew_point(air.temperature, air.humidity), units),
                     name_of(air.origin));
}

std::string findings_as_text(const LogEntry& coat, const Session& session, std::size_t indent) {
  std::string text;
  for (const LoggedFinding& finding : coat.findings) {
    text += finding_as_text(finding, session, indent);
  }
  return text;
}

std::string entry_as_text(const LogEntry& entry, const Session& session) {
  const std::string head = fmt::format("{:>3}  ", entry.id);
  std::string text = wrap(fmt::format("{}{}, {}",
                                      entry.struck() ? "STRUCK OUT: " : "",
                                      deed_of(entry),
                                      show_full(entry.at, session.zone)),
                          head,
                          std::string(kIndent, ' '));
  const auto add = [&text](const std::string& words) {
    text += words.empty() ? "" : wrap(words, kIndent, kIndent + 2);
  };
  if (entry.strike) {
    add(fmt::format(
        "struck out {}: {}", show_full(entry.strike->at, session.zone), entry.strike->why));
  }
  if (!entry.why.empty()) {
    add("because: " + entry.why);
  }
  if (entry.touch) {
    add(touch_words(*entry.touch));
  }
  if (entry.air) {
    add(air_words(*entry.air, session.units));
  }
  text += findings_as_text(entry, session, kIndent);
  add(particulars_of(entry, session.units));
  if (!entry.note.empty()) {
    add("note: " + entry.note);
  }
  return text;
}

nlohmann::ordered_json entry_as_json(const LogEntry& entry, const Session& session) {
  nlohmann::ordered_json whole = {{"number", entry.id},
                                  {"piece", entry.piece},
                                  {"kind", name_of(entry.kind)},
                                  {"step", entry.step},
                                  {"grit", text_or_null(entry.grit)},
                                  {"part", text_or_null(entry.part)},
                                  {"face", text_or_null(entry.face)},
                                  {"product", text_or_null(entry.product)},
                                  {"revision", text_or_null(entry.revision)},
                                  {"at", show_rfc3339(entry.at, session.zone)},
                                  {"amount_l", nullptr},
                                  {"by", text_or_null(entry.by)},
                                  {"batch", text_or_null(entry.batch)},
                                  {"note", text_or_null(entry.note)},
                                  {"why", text_or_null(entry.why)},
                                  {"abraded", entry.abraded},
                                  {"air", nullptr},
                                  {"verdict", nlohmann::ordered_json::array()},
                                  {"logged_at", show_rfc3339(entry.logged_at, session.zone)},
                                  {"struck", nullptr},
                                  {"touch", nullptr},
                                  {"wood_moisture_percent", nullptr},
                                  {"outcome", text_or_null(entry.outcome)},
                                  {"photo", text_or_null(entry.photo)}};
  if (entry.amount) {
    whole["amount_l"] = rounded(entry.amount->litres(), 4);
  }
  if (entry.air) {
    whole["air"] = air_as_json(*entry.air);
  }
  for (const LoggedFinding& finding : entry.findings) {
    whole["verdict"].push_back(finding_as_json(finding, session.zone));
  }
  if (entry.strike) {
    whole["struck"] = {{"why", entry.strike->why},
                       {"at", show_rfc3339(entry.strike->at, session.zone)}};
  }
  if (entry.touch) {
    whole["touch"] = {{"words", entry.touch->words},
                      {"stage", name_of(entry.touch->stage)},
                      {"reached", entry.touch->reached}};
  }
  if (entry.moisture) {
    whole["wood_moisture_percent"] = rounded(100.0 * *entry.moisture, 2);
  }
  return whole;
}

std::string json_page(const nlohmann::ordered_json& whole) {
  using nlohmann::ordered_json;
  return whole.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace coatwright
