#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/fault_trace.h"
#include "plan/piece_state.h"

/// What a log shows of a coat besides its verdict and the air.
namespace coatwright {

/// Something that was off with a coat.
struct FaultMark {
  std::string text;                   ///< What was off, with its figures; part of a sentence.
  bool strong = false;                ///< As of a suspect.
  double by = 0;                      ///< How far off.
  std::string source = {};            ///< May be empty.
  std::optional<double> chance = {};  ///< That it was right all the same.
  std::chrono::seconds off{0};        ///< How late; 0 for others.
};

/// A piece's log read for marks. Points into the case.
class FaultLog {
 public:
  /// @param piece must outlive it.
  explicit FaultLog(const FaultCase& piece) : piece_(piece) {}

  /// The first moment of the log; the epoch where nothing is in it.
  [[nodiscard]] Time begin() const;
  [[nodiscard]] std::vector<const TracedWork*> coats() const;
  /// The coat that a coat went on; null: none that the log knows.
  [[nodiscard]] const TracedWork* beneath(const TracedWork& coat) const;
  /// The coat with its film, dry from its wiping on.
  [[nodiscard]] LaidCoat laid(const TracedWork& coat) const;
  /// @param sign none of a verdict's nor of the air's. @return nothing where the log does not show
  /// it.
  [[nodiscard]] std::optional<FaultMark> mark(FaultSign sign,
                                              const TracedWork& coat,
                                              DryingClocks& clocks) const;

 private:
  [[nodiscard]] const TracedWork* next_coat(const TracedWork& coat) const;
  [[nodiscard]] const TracedWork* wiping(const TracedWork& coat) const;
  /// All coats where a coat is, up to it, the lowest first.
  [[nodiscard]] std::vector<const TracedWork*> coats_up_to(const TracedWork& coat) const;
  [[nodiscard]] bool on_bare_wood(const TracedWork& coat) const;
  [[nodiscard]] const TracedWork* last_before(const TracedWork& coat, StepKind kind) const;

  [[nodiscard]] std::optional<FaultMark> thick_film(const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> much_used(const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> much_in_all(const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> wiped_late(const TracedWork& coat,
                                                    DryingClocks& clocks) const;
  [[nodiscard]] std::optional<FaultMark> early_use(const TracedWork& coat,
                                                   DryingClocks& clocks) const;
  [[nodiscard]] std::optional<FaultMark> of_wood(FaultSign sign, const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> grain_not_raised(const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> sanded_too_fine(const TracedWork& coat) const;
  [[nodiscard]] std::optional<FaultMark> wet_wood(const TracedWork& coat) const;

  const FaultCase& piece_;
};

}  // namespace coatwright
