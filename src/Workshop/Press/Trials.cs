using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Press;

/// <summary>What a workshop has tried: pressed, washed and looked at.</summary>
public static class Trials
{
    /// <summary>Whether a process is new here and no trial stands behind it on a material: neither washed pieces that held, nor figures of the press that rest on a trial.</summary>
    /// <param name="book">The workshop.</param>
    /// <param name="pressing">The process on the material.</param>
    public static bool IsUntried(WorkshopBook book, Pressing pressing)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(pressing);
        return pressing.Process.Untried
            && pressing.Step(StepKind.Press)?.Evidence != Evidence.Trial
            && !book.WashTrials.Any(t =>
                t.Process == pressing.Process.Id && t.Material == pressing.Material.Id && t.Survived > 0
            );
    }
}
