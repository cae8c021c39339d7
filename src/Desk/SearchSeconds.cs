using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk;

/// <summary>How long a search may be told to go on.</summary>
internal static class SearchSeconds
{
    private const double Most = 86_400;

    /// <summary>What is wrong with a limit in seconds; none is right, and so is any up to a day.</summary>
    public static Fault? Wrong(double? seconds) =>
        seconds is null or (> 0 and <= Most)
            ? null
            : new(
                "--seconds",
                $"A number above 0, up to {Most:0} (a day), is needed.",
                "Leave it out for the usual search, which repeats exactly."
            );
}
