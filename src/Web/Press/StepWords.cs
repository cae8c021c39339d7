using Coldpeel.Web.Words;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Web.Press;

/// <summary>The trade's words for the steps, and which of them a clock can count down.</summary>
internal static class StepWords
{
    /// <summary>The trade's word.</summary>
    public static string Name(StepKind kind) =>
        kind switch
        {
            StepKind.Print => PressWords.StepPrint,
            StepKind.Bond => PressWords.StepBond,
            StepKind.HotPeel => PressWords.StepHotPeel,
            StepKind.Trim => PressWords.StepTrim,
            StepKind.PrePress => PressWords.StepPrePress,
            StepKind.Press => PressWords.StepPress,
            StepKind.Cool => PressWords.StepCool,
            StepKind.ColdPeel => PressWords.StepColdPeel,
            StepKind.FinishPress => PressWords.StepFinishPress,
            _ => PressWords.StepInspect,
        };

    /// <summary>What a step's figures rest on.</summary>
    public static string RestsOn(Evidence evidence) =>
        evidence switch
        {
            Evidence.Model => PressWords.RestsModel,
            Evidence.CalibratedModel => PressWords.RestsCalibrated,
            Evidence.Trial => PressWords.RestsTrial,
            _ => PressWords.RestsPractice,
        };

    /// <summary>Whether the seconds belong to a plate or to the air; the others are a hand's own pace, and no bell drives it.</summary>
    public static bool IsTimed(ProcessStep step) =>
        step.Seconds > 0
        && step.Kind is StepKind.Bond or StepKind.PrePress or StepKind.Press or StepKind.Cool or StepKind.FinishPress;

    /// <summary>Whether it is done at the item, not at the sheet.</summary>
    public static bool IsAtItem(StepKind kind) => kind >= StepKind.PrePress;
}
