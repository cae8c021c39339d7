using Coldpeel.Workshop.Press;

namespace Coldpeel.Web.Press;

/// <summary>The trade's words for the steps, and which of them a clock can count down.</summary>
internal static class StepWords
{
    /// <summary>The trade's word.</summary>
    public static string Name(StepKind kind) =>
        kind switch
        {
            StepKind.HotPeel => "Hot peel",
            StepKind.PrePress => "Pre-press",
            StepKind.ColdPeel => "Cold peel",
            StepKind.FinishPress => "Finish press",
            _ => kind.ToString(),
        };

    /// <summary>Whether the seconds belong to a plate or to the air; the others are a hand's own pace, and no bell drives it.</summary>
    public static bool IsTimed(ProcessStep step) =>
        step.Seconds > 0
        && step.Kind is StepKind.Bond or StepKind.PrePress or StepKind.Press or StepKind.Cool or StepKind.FinishPress;

    /// <summary>Whether it is done at the item, not at the sheet.</summary>
    public static bool IsAtItem(StepKind kind) => kind >= StepKind.PrePress;
}
