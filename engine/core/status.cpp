#include "engine/core/status.h"
