using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Coldpeel.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Scarce : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_stock_Least_Count",
                table: "stock");

            migrationBuilder.CreateIndex(
                name: "IX_stock_scarce",
                table: "stock",
                column: "Count",
                filter: "\"Least\" > 0 AND \"Count\" < \"Least\"");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "IX_stock_scarce",
                table: "stock");

            migrationBuilder.CreateIndex(
                name: "IX_stock_Least_Count",
                table: "stock",
                columns: new[] { "Least", "Count" });
        }
    }
}
