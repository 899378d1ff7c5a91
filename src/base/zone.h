#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <date/date.h>

#include "base/result.h"
#include "base/time.h"

namespace date {
class time_zone;
}

namespace coatwright {

using LocalTime = date::local_seconds;

/// An IANA time zone. Cheap to copy. Backed by the system's zone files.
class Zone {
 public:
  /// @param name IANA name such as "America/New_York". Errors: kTime when the system has no such
  /// zone.
  [[nodiscard]] static Result<Zone> find(const std::string& name);
  /// The machine's own zone ($TZ, then /etc/localtime); UTC when it has none.
  [[nodiscard]] static Zone of_machine();

  [[nodiscard]] const std::string& name() const;
  [[nodiscard]] std::chrono::seconds offset_at(Time time) const;
  [[nodiscard]] LocalTime to_local(Time time) const;

  /// @return the moments that show this local time: none in the spring gap, two in the autumn hour.
  [[nodiscard]] std::vector<Time> moments_of(LocalTime local) const;
  /// @return the one moment that shows this local time.
  /// Errors: kTime when it does not exist or exists twice; the message gives both with offsets.
  [[nodiscard]] Result<Time> to_time(LocalTime local) const;
  /// As to_time, but the gap maps to its end and a doubled hour to its first: for shop hours,
  /// where the doors open even on such a night.
  [[nodiscard]] Time to_time_leniently(LocalTime local) const;

 private:
  explicit Zone(const date::time_zone* zone) : zone_(zone) {}
  const date::time_zone* zone_;
};

/// "2027-03-05T16:00:00-05:00" (RFC 3339).
[[nodiscard]] std::string show_rfc3339(Time time, const Zone& zone);
/// "2027-03-05T21:00:00Z".
[[nodiscard]] std::string show_utc(Time time);
/// "Fri 16:00".
[[nodiscard]] std::string show_day_and_time(Time time, const Zone& zone);
/// "16:00".
[[nodiscard]] std::string show_clock(Time time, const Zone& zone);
/// "Fri 5 March 2027".
[[nodiscard]] std::string show_date(Time time, const Zone& zone);
/// "Fri 5 March 2027 16:00".
[[nodiscard]] std::string show_full(Time time, const Zone& zone);
/// "2 d 3 h 20 min", "45 min"; rounded to whole minutes.
[[nodiscard]] std::string show_duration(std::chrono::seconds span);

/// Reads RFC 3339 with offset or Z, as stored and exported. Errors: kTime.
[[nodiscard]] Result<Time> parse_rfc3339(std::string_view text);

}  // namespace coatwright
