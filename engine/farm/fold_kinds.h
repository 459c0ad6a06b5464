// engine/farm/fold_kinds.h -- what the farm looks like after an entry: one function a kind, in the
// fold_*.cpp of its subject. All of them ask that the entry fits or stands on record.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// ---- places ----

void fold(Farm& f, const Event& at, const YardAdded& e);
void fold(Farm& f, const Event& at, const YardChanged& e);
void fold(Farm& f, const Event& at, const YardLost& e);
void fold(Farm& f, const Event& at, const ColonyAdded& e);
void fold(Farm& f, const Event& at, const ColonyChanged& e);
void fold(Farm& f, const Event& at, const ColonyMoved& e);
void fold(Farm& f, const Event& at, const ColonyLost& e);

// ---- kit ----

void fold(Farm& f, const Event& at, const KitAdded& e);
void fold(Farm& f, const Event& at, const KitChanged& e);
void fold(Farm& f, const Event& at, const BatteryChanged& e);
void fold(Farm& f, const Event& at, const BatteryCharged& e);
void fold(Farm& f, const Event& at, const VaporizerCleaned& e);
void fold(Farm& f, const Event& at, const FilterChanged& e);
void fold(Farm& f, const Event& at, const StockReceived& e);
void fold(Farm& f, const Event& at, const AcidDisposed& e);

// ---- season ----

void fold(Farm& f, const Event& at, const CountTaken& e);
void fold(Farm& f, const Event& at, const CoursePlanned& e);
void fold(Farm& f, const Event& at, const CourseChanged& e);
void fold(Farm& f, const Event& at, const CourseEnded& e);
void fold(Farm& f, const Event& at, const CoursesPlanned& e);
void fold(Farm& f, const Event& at, const FreeEveningsSet& e);
void fold(Farm& f, const Event& at, const EveningChanged& e);
void fold(Farm& f, const Event& at, const EveningLost& e);
void fold(Farm& f, const Event& at, const DriveTimeSet& e);
void fold(Farm& f, const Event& at, const AirExpected& e);
void fold(Farm& f, const Event& at, const BroodNoted& e);
void fold(Farm& f, const Event& at, const BoardPutIn& e);
void fold(Farm& f, const Event& at, const ComeBackSettled& e);
void fold(Farm& f, const Event& at, const OtherTreatmentGiven& e);

// ---- the walk ----

void fold(Farm& f, const Event& at, const WalkOpened& e);
void fold(Farm& f, const Event& at, const EnteredLate& e);

// ---- notes, other entries, settings ----

void fold(Farm& f, const Event& at, const NoteWritten& e);
void fold(Farm& f, const Event& at, const EntryStruck& e);
void fold(Farm& f, const Event& at, const EntryCorrected& e);
void fold(Farm& f, const Event& at, const StrikeTakenBack& e);
void fold(Farm& f, const Event& at, const ContradictionSettled& e);
void fold(Farm& f, const Event& at, const YardsJoined& e);
void fold(Farm& f, const Event& at, const ColoniesJoined& e);
void fold(Farm& f, const Event& at, const ClockFollowed& e);
void fold(Farm& f, const Event& at, const SetupChanged& e);
void fold(Farm& f, const Event& at, const SetupKept& e);
void fold(Farm& f, const Event& at, const TabletKeyed& e);
void fold(Farm& f, const Event& at, const TabletTrusted& e);
void fold(Farm& f, const Event& at, const TabletRefused& e);

// Any step of a walk: what it does to the walk, and then to the farm.
void fold_step(Farm& f, const Event& step);

// Changes what is given.
template <class T>
void take(T& field, const std::optional<T>& given) {
  if (given) field = *given;
}

}  // namespace engine
